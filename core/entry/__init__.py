"""The entry line: from typed words to a request, in English and Spanish."""
