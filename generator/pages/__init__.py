"""One small view a page, for one reader. No HTML, no files; from here on nothing is computed."""
