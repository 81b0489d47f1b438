### What the view of the order of use says.

order-title = Order of use
order-nothing = Nothing is planned yet. Place a site in the arch.
