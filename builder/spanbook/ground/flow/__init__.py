"""What flows through a network of ways: pressures, flows, and how far both can lie.

Everything here is in SI units: pascal, cubic metre a second, metre, pascal second, kilogram a cubic metre.
For direct current the same holds of volts, amperes and ohms. Left out: pulsation, cavitation, heat and
gases, whose density changes with pressure.
"""
