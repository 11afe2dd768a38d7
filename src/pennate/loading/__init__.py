"""From a target to iron: every load on the equipment a gym really has."""
