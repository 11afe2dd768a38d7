"""Tests of turning targets into iron."""
