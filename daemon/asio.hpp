#pragma once
// Boost 1.74's coroutine headers use std::exchange without including <utility>; this is the only
// way to Asio.
#include <boost/asio/io_context.hpp>
#include <boost/asio/post.hpp>
#include <boost/asio/signal_set.hpp>
#include <boost/asio/steady_timer.hpp>
#include <boost/asio/thread_pool.hpp>
#include <utility>
