"""From files to the model: the only floor that opens YAML."""
