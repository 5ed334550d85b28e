"""What each setting should be: a window with reasons, for one system or a whole fleet."""
