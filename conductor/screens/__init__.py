"""The screens: the one room that knows textual. It draws a class that is handed in."""
