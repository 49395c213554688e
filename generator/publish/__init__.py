"""The outside world: HTML, sites, codes and files. The only door to Jinja, MkDocs and the QR library."""
