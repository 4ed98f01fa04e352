"""The parts the screens are made of."""
