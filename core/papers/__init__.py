"""Papers to print and to hand on: one page of HTML, a folder of tables."""
