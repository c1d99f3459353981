"""What passes between the stages of cuewright; depends on pydantic alone."""
