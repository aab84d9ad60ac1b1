"""What people do, one function a deed, and the views that faces show."""
