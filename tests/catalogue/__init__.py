"""The catalogue, its cautions, the evidence register and the published 1RM equations."""
