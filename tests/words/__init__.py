"""The catalogue of sentences, held against the code that says them."""
