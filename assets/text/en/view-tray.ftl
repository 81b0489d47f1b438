### What the view of the tray says.

tray-title = Tray
tray-none = The case has no tray. Choose one in the case.
tray-row = { $number }. { $name }, { $slot }
tray-row-set = { $number }. { $name }, { $slot }: { $setting }
