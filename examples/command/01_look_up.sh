# Look up a feedstock: what is known of used coffee grounds, how well, and from where.
feed show "coffee grounds" --numbers
