"""The figure of a class: its time as lanes of stretches, drawn as text or as a picture."""
