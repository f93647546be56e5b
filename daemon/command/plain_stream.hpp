#pragma once
#include <iosfwd>
#include <ostream>
#include <streambuf>
#include <string>

namespace gley::daemon {

/// Passes lines on with everything in them that could command a terminal, or turn a reader's eye,
/// made into '?': what a command says may quote its own options, files and what came over MQTT.
class PlainStream final : public std::ostream {
 public:
  /// The other stream must outlive this one.
  explicit PlainStream(std::ostream& target);
  ~PlainStream() override;
  PlainStream(const PlainStream&) = delete;
  PlainStream& operator=(const PlainStream&) = delete;

 private:
  class Buffer final : public std::streambuf {
   public:
    explicit Buffer(std::ostream& out) : out_(out) {}
    void pass_on();

   protected:
    int_type overflow(int_type next) override;
    int sync() override;

   private:
    std::ostream& out_;
    std::string text_;
  };
  Buffer buffer_;
};

}  // namespace gley::daemon
