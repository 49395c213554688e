"""What those who build and those who issue both need of folders: one run at a time, archives, and what earlier issues left."""
