"""quizkit: training and clearance quizzes for people who dispense two-part repair materials.

Importing the package is light: a room is imported when it is used.
"""

__version__ = "0.1.0"
