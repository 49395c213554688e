"""Where units hang in the house; what is seen, heard and walked there."""
