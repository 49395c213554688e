"""The keys of every file stood in tables of the README; they stand in the manual now. This leaves a README as it is."""

if __name__ == "__main__":
    print("The keys stand in the manual: doorpost manual --out DIR. Nothing was changed.")
