"""What leaves for other programs and comes from them: tables, calendars, statements, signed files, lists of people.

Everything is made from plain values of views, and nothing here opens a shop.
"""
