"""Run the counter with `python -m counter`."""

from counter.cli.main import main

raise SystemExit(main())
