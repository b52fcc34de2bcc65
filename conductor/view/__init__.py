"""The one picture of a class that every front end draws from, and how large its letters are."""
