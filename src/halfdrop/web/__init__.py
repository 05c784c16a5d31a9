"""The workbench in a browser: an ASGI application over the services; owns no arithmetic."""
