"""May it be treated: what it tolerates, what is still to be asked, what it may do to the person."""
