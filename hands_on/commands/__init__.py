"""What each command does; imported only when it is called. None of the computing ones needs textual."""
