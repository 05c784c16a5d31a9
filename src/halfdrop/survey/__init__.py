"""Tape to outline: adjusted corners with their covariance, and what is wrong with the measures."""

from halfdrop.survey.result import ExpectedReading, ExtraMeasure, ObservationResult, SurveyResult, Suspect
from halfdrop.survey.room_survey import adjust_survey

__all__ = ["ExpectedReading", "ExtraMeasure", "ObservationResult", "SurveyResult", "Suspect", "adjust_survey"]
