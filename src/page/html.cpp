#include "page/html.hpp"

#include <cstdint>

#include <zlib.h>

#include "diag/fault.hpp"
#include "exchange/sha256.hpp"
#include "units/letters.hpp"

namespace fallwright::page {
namespace {

/// How a policy names a script or a style: the fingerprint's bytes in base 64.
std::string fingerprint(std::string_view text) {
  const std::string digits = exchange::sha256(text);
  std::string bytes;
  for (std::size_t i = 0; i < digits.size(); i += 2)
    bytes += static_cast<char>(std::stoi(digits.substr(i, 2), nullptr, 16));
  return "'sha256-" + base64(bytes) + "'";
}

/// "'none'" where there is nothing to name.
std::string all_of(const std::string& names) {
  return names.empty() ? " 'none'" : names;
}

/// Nothing from outside: no script, style, picture, form or request. Files that are saved are made in the page.
std::string policy_of(const Document& document) {
  std::string scripts;
  for (const std::string_view script : document.scripts) scripts += " " + fingerprint(script);
  return "default-src 'none'; script-src" + all_of(scripts) + "; style-src " + fingerprint(document.style) +
         "; img-src data: blob:; base-uri 'none'; form-action 'none'";
}

std::string head_of(const Table& table) {
  std::string head;
  for (const std::string& words : table.head) head += element("th", words, " scope=\"col\"");
  return element("thead", element("tr", head));
}

}  // namespace

std::string escaped(std::string_view text) {
  std::string out;
  for (const char c : units::on_one_line(text)) switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      case '\'':
        out += "&#39;";
        break;
      default:
        out += c;
    }
  return out;
}

std::string named(std::string_view text) {
  return element("bdi", escaped(text));
}

std::string element(std::string_view name, std::string_view inner, std::string_view attributes) {
  std::string text = "<";
  text.append(name).append(attributes).append(">").append(inner).append("</").append(name).append(">");
  return text;
}

std::string html_of(const Table& table) {
  std::string rows;
  for (std::size_t i = 0; i < table.rows.size(); ++i) {
    std::string row;
    for (std::size_t k = 0; k < table.rows[i].size(); ++k) {
      const Cell& cell = table.rows[i][k];
      const std::string sort = cell.sort.empty() ? "" : " data-sort=\"" + escaped(cell.sort) + "\"";
      row += k == 0 ? element("th", cell.html, " scope=\"row\"" + sort) : element("td", cell.html, sort);
    }
    rows += element("tr", row, i < table.row_attributes.size() ? table.row_attributes[i] : "") + "\n";
  }
  return element("div",
                 element("table", element("caption", table.caption) + head_of(table) + element("tbody", "\n" + rows),
                         " id=\"" + table.id + "\""),
                 " class=\"scroll\" tabindex=\"0\" role=\"region\" aria-label=\"" + table.caption + "\"") +
         "\n";
}

std::string html_of(const Document& document) {
  std::string text = "<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n";
  text += "<meta http-equiv=\"Content-Security-Policy\" content=\"" + policy_of(document) + "\">\n";
  text += "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n";
  text += "<meta name=\"color-scheme\" content=\"light dark\">\n";
  text += element("title", escaped(document.title)) + "\n<style>" + std::string{document.style} + "</style>\n</head>\n";
  text += "<body>\n" + document.body;
  for (const auto& [id, data] : document.data)
    text += element("script", data, " type=\"application/json\" id=\"" + id + "\"") + "\n";
  for (const std::string_view script : document.scripts) text += element("script", script) + "\n";
  return text + "</body>\n</html>\n";
}

std::string data_of(const Json& json) {
  std::string out;
  for (const char c : json.dump(-1, ' ', /*ensure_ascii=*/true, Json::error_handler_t::replace)) switch (c) {
      case '<':
        out += "\\u003c";
        break;
      case '>':
        out += "\\u003e";
        break;
      case '&':
        out += "\\u0026";
        break;
      default:
        out += c;
    }
  return out;
}

std::string base64(std::string_view bytes) {
  constexpr char letters[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string out;
  out.reserve((bytes.size() + 2) / 3 * 4);
  for (std::size_t i = 0; i < bytes.size(); i += 3) {
    const auto byte = [&](std::size_t k) {
      return i + k < bytes.size() ? static_cast<std::uint32_t>(static_cast<unsigned char>(bytes[i + k])) : 0u;
    };
    const std::uint32_t group = byte(0) << 16 | byte(1) << 8 | byte(2);
    out += letters[group >> 18 & 63];
    out += letters[group >> 12 & 63];
    out += i + 1 < bytes.size() ? letters[group >> 6 & 63] : '=';
    out += i + 2 < bytes.size() ? letters[group & 63] : '=';
  }
  return out;
}

std::string packed(std::string_view bytes) {
  uLongf size = compressBound(bytes.size());
  std::string out(size, '\0');
  const int told = compress2(reinterpret_cast<Bytef*>(out.data()), &size, reinterpret_cast<const Bytef*>(bytes.data()),
                             bytes.size(), Z_BEST_COMPRESSION);
  diag::ensure(told == Z_OK, "bytes of a page could not be packed");
  out.resize(size);
  return base64(out);
}

}  // namespace fallwright::page
