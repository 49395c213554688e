"""The company's record, document by document."""
