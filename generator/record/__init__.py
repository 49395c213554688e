"""Files beside the job: what is written there for people to go on with."""
