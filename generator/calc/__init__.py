"""Pure calculations: papers in, one frozen result out. No files, no clock, no chance."""
