"""Every rule of the audit, one a file, discovered by `halfdrop.audit.rule`."""
