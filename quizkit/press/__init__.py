"""What is printed or built ahead: a static page a lesson, the author's previews, paper checks and sheets."""
