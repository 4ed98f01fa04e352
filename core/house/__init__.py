"""What a house says of itself: leaf, blends, vitolas, approved bunches, benches."""
