# The frame of each page of the site.
frame-skip = Skip to the page's text
frame-main = Main
frame-here = You are here
frame-start = By date
frame-jobs = Jobs
frame-machines = Machines
frame-procedures = Procedures
frame-records = Records
frame-search = Search
frame-to = to
frame-table = Table: { $name }
frame-limits = The check of the plant's files shows that the written procedures are complete and in order, but for the exceptions a packet names. It does not show that a machine is safe, that its list of energy sources is right, or that a lock is on.
frame-data = Data of the plant (SHA-256)
frame-plant = Plant
frame-made = Made by
frame-parts = Drawn with
frame-parts-link = Parts of these pages
