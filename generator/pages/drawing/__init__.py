"""What the drawings of storeys and plot show, in metres of the plan."""
