"""The programme at a second: what stands, what fits, what is lost, in words."""
