"""One working day: its entries, what they add up to, and where the leaf went."""
