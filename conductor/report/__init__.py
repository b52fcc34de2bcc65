"""What commands print: the score as a table, findings and rules as text and as JSON."""
