/// Rooms that nobody listed: a whole job file from a seed, its mirror image, and its twin in the other unit.
#pragma once

#include <cstddef>
#include <string>

namespace fallwright::sample {

/// A job file, in inches, that the reader takes: surveyed or as designed, any place of the bench or none, any drain and
/// underside, walls on two or three sides, readings as set. In it every bare decimal number is a length in `job.unit`,
/// and no default is left that depends on the unit. The same seed makes the same text.
/// The back wall's studs are read, or stand at whole parts of its width: laid out from its left corner, others have no
/// mirror.
std::string random_room(unsigned seed);

/// Such a room with a base of another kind, "bought" or "site-built", with readings and choices of its own at random.
std::string random_room_of(const std::string& kind, unsigned seed);

/// A room as designed with its base as a STEP file in place of all that the file tells of it.
std::string with_base_file(const std::string& job_file, const std::string& step);

/// The same room seen in a mirror that stands along the depth. `job_file`: as `random_room` makes them.
std::string mirrored(const std::string& job_file);
/// The same room, whose job says that the first joist was read level with its drain: a base from a file has its drain a
/// hair elsewhere, and joists stay where they are.
std::string with_first_joist_placed(const std::string& job_file);

/// x of a point and x of its mirror image add up to this: the length of the back wall as it is solved.
double mirror_axis_mm(const std::string& job_file);

/// The same room with nothing in it rounded to a mark of the tape, which is another in each unit: pieces exact, a gauge
/// depth of its own.
std::string without_tape(const std::string& job_file);

/// The same room written in the other unit, each length to the last bit the same.
std::string in_millimetres(const std::string& job_file);

/// The same room under other names: the job's, its fixtures', and those of materials.
std::string renamed(const std::string& job_file);

/// The same room with all spot levels, and all readings as set, taken from another level line, so much lower.
std::string with_lower_line(const std::string& job_file, double by);

/// The same room with a length of it ("bed.least") greater by so much, in the job's unit.
std::string with_more(const std::string& job_file, const std::string& key, double by);

/// The same room with one line of its file changed or added: a key and its value in TOML; no value takes it out. Of a
/// section that stands several times the entry of that number.
std::string with_line(const std::string& job_file, const std::string& key, const std::string& value,
                      std::size_t entry = 0);

}  // namespace fallwright::sample
