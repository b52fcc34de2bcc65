"""The check: what would go wrong in front of the room, found before anybody stands on a mat."""
