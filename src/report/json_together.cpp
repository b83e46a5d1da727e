#include "report/json_takeoff.hpp"
#include "report/together.hpp"

namespace fallwright::report {
namespace {

Json room(const Room& r) {
  if (!r.failure.empty()) return {{"name", r.name}, {"failure", r.failure}};
  return {{"name", r.name},
          {"hand", r.hand},
          {"base", r.base},
          {"bed_set_mm3", r.set_mm3},
          {"batches", r.batches},
          {"cost", maybe(r.cost)},
          {"worst", {{"id", r.worst.id}, {"result", rules::name_of(r.worst.outcome)}}}};
}

Json packs(const takeoff::Pooled& p) {
  Json json = row_json(p.row);
  json["rooms"] = p.rooms;
  json["buy_apart"] = p.apart;
  return json;
}

Json piece(const takeoff::SawRow& p) {
  Json json = cut_json(p.cut);
  json.erase("part_ids");
  json["owners"] = list(p.owners, [](const takeoff::Owner& o) {
    return Json{{"room", o.room + 1}, {"mark", o.mark}, {"count", o.count}};
  });
  return json;
}

}  // namespace

std::string to_json(const Together& all) {
  Json json;
  json["schema"] = 1;
  json["tool"] = {{"name", "fallwright"}, {"version", version()}};
  json["rooms"] = list(all.rooms, room);
  json["takeoff"] = list(all.packs, packs);
  json["cost"] = cost_json(all.priced ? all.cost : takeoff::Cost{}, all.currency);
  json["cost_apart"] = maybe(all.cost_apart);
  json["cuts"] = list(all.pieces, piece);
  json["stocks"] = list(all.plan, stock_json);
  json["sticks"] = sticks_json(all.plan);
  json["kits"] = list(all.kits, [](const takeoff::Kit& k) {
    return Json{{"length_mm", k.length_mm}, {"rooms", k.rooms}};
  });
  json["tightest"] = list(all.tightest, [](const Tightest& t) {
    return Json{{"id", t.result.id},
                {"result", rules::name_of(t.result.outcome)},
                {"margin", maybe(t.result.margin)},
                {"room", t.room}};
  });
  json["files"] = list(all.files, [](const File& f) {
    return Json{{"path", f.path}, {"bytes", f.bytes}, {"sha256", f.sha256}};
  });
  return dumped(json);
}

}  // namespace fallwright::report
