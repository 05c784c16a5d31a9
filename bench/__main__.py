"""Run every measurement."""

from bench import audit, rolls

audit.main()
rolls.main()
