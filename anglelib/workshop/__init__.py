"""The workshop: a class for a day, from its stock to its sign-off."""
