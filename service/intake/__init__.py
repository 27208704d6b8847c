"""From what a designer wrote to a Brief in SI and plane coordinates, every assumption listed."""

from service.intake.drawing import drawn_roof
from service.intake.reading import read_brief
from service.intake.weather import read_weather_file

__all__ = ["drawn_roof", "read_brief", "read_weather_file"]
