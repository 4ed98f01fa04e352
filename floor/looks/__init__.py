"""How the floor looks: inks, shapes, big figures, words; no desk and no keys."""
