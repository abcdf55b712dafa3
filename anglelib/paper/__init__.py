"""What is printed for the bench: templates at 1:1, cards, plan pages, and the pack that holds them."""
