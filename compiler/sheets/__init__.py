"""Everything printed or shown, made from the plan alone."""
