#!/usr/bin/env python3
"""A small subscriber that commits with synchronous=FULL before it acknowledges: each reading, or with "gathered" what came in one go.

Speaks just enough MQTT 3.1.1 to need nothing but the standard library. Usage: subscriber.py PORT DATABASE each|gathered
"""
import socket
import sqlite3
import struct
import sys


def text(value):
    data = value.encode()
    return struct.pack(">H", len(data)) + data


def packet(kind, body):
    length, head = len(body), bytearray([kind])
    while True:
        length, byte = length >> 7, length & 0x7F
        head.append(byte | (0x80 if length else 0))
        if not length:
            return bytes(head) + body


def packets(data):
    """Takes whole packets off the front of a buffer."""
    while len(data) >= 2:
        length, shift, at = 0, 0, 1
        while True:
            if at >= len(data):
                return
            byte = data[at]
            length |= (byte & 0x7F) << shift
            shift, at = shift + 7, at + 1
            if not byte & 0x80:
                break
        if len(data) < at + length:
            return
        yield data[0], bytes(data[at:at + length])
        del data[:at + length]


def main(port, path, is_gathered):
    database = sqlite3.connect(path, isolation_level=None)
    database.execute("PRAGMA journal_mode=WAL")
    database.execute("PRAGMA synchronous=FULL")
    database.execute("CREATE TABLE IF NOT EXISTS readings(topic TEXT, payload TEXT)")
    broker = socket.create_connection(("127.0.0.1", port))
    broker.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
    broker.sendall(packet(0x10, text("MQTT") + bytes([4, 0]) + struct.pack(">H", 0) + text("store")))
    broker.sendall(packet(0x82, struct.pack(">H", 1) + text("curewatch/#") + bytes([1])))
    data = bytearray()
    while True:
        chunk = broker.recv(65536)
        if not chunk:
            return
        data += chunk
        rows, acknowledgements = [], bytearray()
        for kind, body in packets(data):
            if kind >> 4 != 3:
                continue
            (length,) = struct.unpack_from(">H", body)
            topic, rest = body[2:2 + length].decode(), body[2 + length:]
            if kind & 0x06:
                acknowledgements += packet(0x40, rest[:2])
                rest = rest[2:]
            rows.append((topic, rest.decode()))
            if not is_gathered:
                store(database, broker, rows, acknowledgements)
        if rows:
            store(database, broker, rows, acknowledgements)


def store(database, broker, rows, acknowledgements):
    database.execute("BEGIN")
    database.executemany("INSERT INTO readings VALUES(?, ?)", rows)
    database.execute("COMMIT")
    broker.sendall(acknowledgements)
    rows.clear()
    acknowledgements.clear()


main(int(sys.argv[1]), sys.argv[2], sys.argv[3] == "gathered")
