"""What people and programs call: wiring, no logic."""
