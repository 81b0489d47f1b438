### What the start page says.

start-title = Prepare a case
start-job = From the plan to every depth stop, the loaded tray and the signed checklist.
start-new = New case
start-reference = Case reference, not a name
start-jaw = Jaw
start-support = Guide support
start-support-teeth = teeth
start-support-teeth-and-mucosa = teeth and mucosa
start-support-mucosa = mucosa
start-support-bone = bone
start-access = Access to the bone
start-access-flap = a full-thickness flap
start-access-punch = a tissue punch
start-pick = choose
start-kit = Instruments from: { $kit }
start-invented-kit = the invented kit Hedgerow
start-practice = An invented kit: the case will be for practice and say so on every page.
start-fill = Still needed to begin: { $list }
start-fill-code = a reference
start-fill-jaw = the jaw
start-fill-support = the guide support
start-fill-access = the access to the bone
start-begin = Begin
start-choose-kit = Use instruments from another kit…
start-open = Existing case
start-choose-file = Open a case file…
start-drop = or drop the file onto the window
start-recent = Recent
start-practise = Practise
start-practise-what = Invented cases. Nothing done on them counts for a patient.
demo-one-premolar = A lower premolar, everything known
demo-two-molars = Two lower molars over the canal
demo-full-arch-upper = An edentulous upper jaw, six implants
demo-fixed-stops = Fixed stops, and a site without a stop
demo-upper-face-gauge = A gauge that reads the upper face
demo-fresh-socket = A fresh socket, only the pilot drill guided
demo-one-figure = One figure for a sequence

## Cases of a folder

start-beside = Cases in { $folder }
start-find = Find by reference, tooth or file
start-beside-reading = The folder is being read.
start-beside-none-found = None of the { $count } cases has these words.
listed-none = No case files in { $folder }
listed-newer = written by a newer version of this program; it cannot be opened here
listed-damaged = not to be read as a case; open it to see what is wrong and where
listed-no-sites = no site yet
listed-revision = revision { $revision }
listed-changed = changed { $at }
listed-demonstration = demonstration
