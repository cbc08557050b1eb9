"""Ways of saying made even in a row's text, letter for letter as long as before."""
