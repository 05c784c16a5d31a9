"""`python -m halfdrop` is the `halfdrop` command."""

from halfdrop.cli import main

if __name__ == "__main__":
    main()
