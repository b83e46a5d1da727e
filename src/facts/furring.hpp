/// What furring strips make good.
#pragma once

namespace fallwright::facts {

/// Furring brings framing so far forward, and no farther, as a fastener's hold. Common practice, no source.
inline constexpr double most_furring_mm = 38.1;

/// Nobody rips a strip thinner than that, about 1/4 in: it breaks or is thrown by the saw. What is thinner is shimmed
/// with tapered pairs or with strips of card in layers. Common practice, no source.
inline constexpr double least_ripped_mm = 6;

}  // namespace fallwright::facts
