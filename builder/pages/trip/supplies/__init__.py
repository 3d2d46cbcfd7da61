"""What goes along: food, water, fuel, packs, what to buy and what to dry."""
