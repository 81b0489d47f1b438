### The run order: why no order is possible. No capital at the start, no full stop at the end.

order-no-copy = there is no { $tool }, which step { $step } at { $site } needs. Give it at least one copy, or let the step use another tool
order-no-piece = there is no piece of the sleeve { $sleeve }, which step { $step } at { $site } needs. Give it at least one piece, or let the step use another sleeve
order-falling = step { $step } at { $site } is narrower than the drilling step before it, which contradicts the rule by_diameter. Leave the rule out, or put the steps in another order
order-contradiction = the rules contradict each other, because they lead in a circle: { $circle }. Leave one of them out
order-too-large = { $sites } sites with { $steps } steps are more than the { $most_sites } sites and { $most_steps } steps that a problem can have. Split the problem
