// core/apart.h - marks functions that the page's first picture never calls.
//
// The build cuts core.wasm in two at them (web/split-core.mjs): what is reached through them
// alone comes with core-more.wasm, later. Such a function is called only behind a condition that
// cannot hold before that: a layer that is off at first, a flight by hand, a part of the report
// that was asked for.
#pragma once

/// Kept as a function of its own, and by its name.
#define CORE_APART [[gnu::noinline, gnu::used]]
