"""Ways through several questions and screens; called by the program alone, through `tui.routes`."""
