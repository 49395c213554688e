"""What is sent to the monitoring station, by which ways, and which calls the day makes."""
