"""The face in the browser: one blueprint a role, thin views over the deeds and views of the shop."""

from quizkit.web.app import create_app

__all__ = ["create_app"]
