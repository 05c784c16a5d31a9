"""Run every measurement."""

from bench import audit

audit.main()
