"""The color trade: spaces, differences, notation, lights, pictures, swatches, and measures of a room's colors.

Nothing is loaded here: name the module. What needs colour-science loads it when it is first asked for.
"""
