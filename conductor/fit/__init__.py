"""What joins compiling, checking and timing: classes and plans made to fit a time. Pure."""
