"""An invented house, and two weeks of working days simulated in its rolling room."""
