"""The tests: one folder a room."""
