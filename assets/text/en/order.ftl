### The run order: why no order is possible. No capital at the start, no full stop at the end.

order-no-copy = there is no { $tool }, which step { $step } at { $site } needs. Provide at least one copy, or use another tool for the step
order-no-piece = there is no sleeve { $sleeve }, which step { $step } at { $site } needs. Provide at least one, or use another sleeve for the step
order-falling = step { $step } at { $site } is narrower than the drilling step before it, which contradicts the rule by_diameter. Leave the rule out, or reorder the steps
order-contradiction = the rules contradict each other in a circle: { $circle }. Leave one of them out
order-too-large = { $sites } sites with { $steps } steps are more than the { $most_sites } sites and { $most_steps } steps that a problem can have. Split the problem
