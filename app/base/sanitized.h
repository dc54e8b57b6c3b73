// Whether this is a build under a sanitizer, which reserves terabytes of address space, reads files
// for its reports and refuses great allocations by itself: some limits are another's then.
// ThreadSanitizer besides holds locks of its own while a process or thread is being made: what is
// stopped by a signal then never comes to its end.
#pragma once

namespace fettle {

#if defined(FETTLE_SANITIZED)
inline constexpr bool kSanitized = true;
#else
inline constexpr bool kSanitized = false;
#endif

#if defined(__has_feature)
inline constexpr bool kSeeksRaces = __has_feature(thread_sanitizer);
#else
inline constexpr bool kSeeksRaces = false;
#endif

} // namespace fettle
