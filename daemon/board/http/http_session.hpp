#pragma once
#include <boost/asio/ip/tcp.hpp>
#include <memory>
#include <set>
#include <string>

#include "daemon/asio.hpp"
#include "daemon/board/http/http_answer.hpp"
#include "daemon/board/http/http_server.hpp"

namespace gley::daemon {

class Connection;

/// What the server's listener and its connections share.
struct HttpShared {
  HttpShared(HttpServer::Handler handler, const HttpLimits& http_limits)
      : limits(http_limits),
        callers(http_limits.caller),
        answerer(std::move(handler), callers, refusals) {}

  HttpLimits limits;
  bool open = true;
  Callers callers;
  HttpRefusals refusals;
  HttpAnswerer answerer;
  std::set<Connection*> connections;
  std::set<Connection*> event_clients;
  std::shared_ptr<const std::string> last_event;
};

/// Takes a connection over for as long as it lives, or closes it if that is over a limit.
void admit(boost::asio::ip::tcp::socket socket, const std::shared_ptr<HttpShared>& shared);

void close_all(HttpShared& shared);
void send_to_event_clients(HttpShared& shared, const std::shared_ptr<const std::string>& text);

}  // namespace gley::daemon
