"""The rugs rules."""
