## Rules of who is there for a job.
person-without-role = { $name } has no role on { $day }
    .way-out = name people who hold a role on that day, or give { $name } one in people.yaml
crew-not-there = `{ $id }` works under the lockout of this job, and is not among its people
    .way-out = add `{ $id }` to `people` of the job, or take `{ $id }` out of `crew`: a plan that does not know who has a lock on is wrong (29 CFR 1910.147(f)(3)(ii)(B))
