"""The report: what somebody found on one machine, told by taps, with pictures, handed over as a packet."""
