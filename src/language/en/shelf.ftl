# What to fetch, by the place where it lies: the list of one job and that of a shift.
shelf-title = What to fetch
shelf-use = Fetch everything before the line stops, place by place. Tick a thing when it is on the cart. Look at the date of each instrument: do not measure with one whose calibration is over. Keep new material outside the marked area of the line until the step that brings it in.
shelf-here = At the machine: nothing to fetch
shelf-unknown = Nobody says where it lies
shelf-other = Other things
shelf-none = The packets of this shift ask for nothing to be fetched.
shelf-box = On the cart
shelf-what = What
shelf-jobs = For which job, needed when
shelf-is-here = at the machine already
shelf-for-stop = by the stop
shelf-before-stop = before the stop, step { $step }
shelf-for-step = step { $step }
shelf-counted = { $count } × { $item }
shelf-too-few = There are too few of { $item }: { $count }. Wanted are { $wanted }, by { $jobs }: { $when }.
