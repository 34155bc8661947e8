from tests.hostile.fuzz_records import FUZZER as FUZZER
