### What the view findings says.

findings-title = Findings
findings-all = All
findings-back-to-surgery = Back to surgery, to the same step ({ $key })
findings-open = Open
findings-where = Where
findings-anywhere = anywhere
findings-whole-case = the case as a whole
findings-about = About
findings-any-subject = anything
findings-subject-clearance = clearances
findings-subject-instrument = instruments
findings-subject-stock = stock and tray
findings-subject-sequence = sequences
findings-subject-guide = the guide
findings-none = Nothing of this kind.
findings-group = { $word }: { $count }
findings-list-clear = List them
findings-count-clear = Only count them
# Beneath a cause on which several findings hang
findings-unfold = list them
findings-fold = fold them away

## One finding

findings-remedy = What to do
findings-go = Go to { $view }
findings-go-to-place = Go to { $view }, { $place }
findings-go-key = Enter
findings-came-about = How it was calculated

## The surgeon's decision

findings-word = Surgeon's decision
findings-lapsed = Decision that does not count
findings-take-back = Withdraw it
findings-drop-lapsed = Remove it
findings-not-acceptable = No reason can settle it: it stays open until it is resolved.
findings-accept-heading = Accept it
findings-accept-what = The reason is printed beside the finding and holds as long as the finding stays the same. It does not make it clear.
findings-reason = Reason
findings-by = Name of the surgeon
findings-fill = A name is needed, and a reason of at least two words and ten letters
findings-accept = Accept with this reason
findings-intend = It is intended
findings-undo-accept = accepted: { $what }
findings-undo-intend = intended: { $what }
findings-undo-take-back = decision withdrawn: { $what }

## Look-alikes

findings-look-alikes = Look-alikes on the tray
findings-look-alikes-what = What another drill, setting or sleeve of this tray would do if it were taken by mistake.
findings-look-alikes-none = None of the mix-ups that were tried, with the settings and sleeves of this case, would break a limit.
