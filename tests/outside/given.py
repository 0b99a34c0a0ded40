"""Trips that several tests stand on; invented."""

LEDGE = """title: Otter ledge
starts: 2027-06-04
people: {learners: 3, instructors: 1}
stove: canister on top
water_treatment: filter
camps: [{name: Otter ledge, nights: 1, elevation: 900 m}]
"""
