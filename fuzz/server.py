"""Sends malformed and odd edits to a running server and watches that it stays well.

    ringwright open FOLDER --no-browser --port 7470      # prints ADDRESS
    python3 fuzz/server.py ADDRESS PROJECT SECONDS

Only against 127.0.0.1. Prints requests, answers by status, and what went wrong: a
connection that ends without an answer, a status of 500 or more, a project's file that
can no longer be read, or an address that tells more than it should.
"""

import collections
import http.client
import json
import random
import sys
import time
import urllib.parse

address, project, seconds = sys.argv[1], sys.argv[2], float(sys.argv[3])
url = urllib.parse.urlparse(address)
assert url.hostname == "127.0.0.1", "only this machine"
rng = random.Random(7)


def connect():
    return http.client.HTTPConnection(url.hostname, url.port, timeout=30)


door = connect()
door.request("GET", "/?" + url.query)
welcome = door.getresponse()
welcome.read()
cookie = welcome.getheader("set-cookie").split(";")[0]
HEAD = {"Cookie": cookie, "Content-Type": "application/json"}
link = connect()


def ask(method, path, body=None, head=HEAD):
    global link
    try:
        link.request(method, path, body, head)
        answer = link.getresponse()
        data = answer.read()
        if answer.getheader("connection") == "close":
            link.close()
            link = connect()
        return answer.status, data
    except (OSError, http.client.HTTPException) as error:
        link.close()
        link = connect()
        return repr(error), b""


PIECE = "/api/piece/" + urllib.parse.quote(project)
status, data = ask("GET", PIECE)
assert status == 200, (status, data[:200])
view = json.loads(data)
paths = list(view["blanks"]) + ["section", "form.outer", "section[0].ring", "section[1].band", "woods.x.density"]
words = ["", "0", "-1", "1e308", "nan", "inf", "3 1/8 in", "auto", "half", "corner", "padauk", "\u0000",
         "9" * 300, "½", "6,5 mm", "\"", "]]", "[[section]]", "#", "\n[x]\n", "\u202e", "true", "1/0", "%s", "../.."]


def value(depth=0):
    kind = rng.randrange(9)
    if kind == 0:
        return None
    if kind == 1:
        return rng.random() < 0.5
    if kind == 2:
        return rng.choice([0, -1, 1e308, -1e-308, 2**63, 0.1, 12, 360, rng.uniform(-500, 500)])
    if kind == 3 and depth < 4:
        return [value(depth + 1) for _ in range(rng.randrange(6))]
    if kind == 4 and depth < 4:
        return {rng.choice(words): value(depth + 1)}
    if kind == 5:
        return str(round(rng.uniform(0, 200), 1))
    return rng.choice(words)


def path():
    text = rng.choice(paths)
    for _ in range(rng.randrange(3)):
        at = rng.randrange(len(text) + 1)
        text = text[:at] + rng.choice(["", "[", "]", ".", "#", "[99]", "x", "\u0000", "[\"", "0"]) + text[at + rng.randrange(2):]
    return text


def edit():
    op = rng.choice(["set", "set", "set", "add", "remove", "move", "burn"])
    out = {"op": op, "path": path() if rng.random() < 0.6 else rng.choice(paths)}
    if op in ("set", "add") or rng.random() < 0.1:
        out["value"] = value()
    if op == "add":
        out["at"] = rng.choice([0, 1, 2, 99, 2**31, -1])
    if op == "move":
        out["to"] = rng.choice([0, 1, 2, 99, 2**32 - 1, "x"])
    return out


def body():
    text = json.dumps({
        "edits": [edit() for _ in range(rng.randrange(1, 4))],
        "base": view["version"] if rng.random() < 0.9 else "no such",
        "preview": rng.random() < 0.7,
    })
    data = bytearray(text.encode())
    if rng.random() < 0.4:
        for _ in range(rng.randrange(1, 6)):
            at = rng.randrange(len(data))
            change = rng.randrange(3)
            if change == 0:
                data[at] = rng.randrange(256)
            elif change == 1:
                del data[at:at + rng.randrange(8)]
            else:
                data[at:at] = bytes(rng.randrange(256) for _ in range(rng.randrange(8)))
            if not data:
                break
    return bytes(data)


tally, wrong = collections.Counter(), []
end = time.time() + seconds
while time.time() < end:
    sent = body()
    target = rng.choice(["/edit", "/edit", "/edit", "/edit", "/take", "/text", "/undo", "/redo"])
    status, data = ask("POST", PIECE + target, sent)
    tally[status] += 1
    if not isinstance(status, int) or status >= 500:
        wrong.append((target, status, sent[:300], data[:200]))
    if sum(tally.values()) % 50 == 0:
        status, data = ask("GET", PIECE)
        if status == 200:
            now = json.loads(data)
            view["version"] = now["version"]
            if now["problems"]:
                wrong.append(("the file", now["problems"]))
        else:
            wrong.append(("view", status, data[:200]))
print(sum(tally.values()), "requests;", dict(tally))
print(len(wrong), "wrong")
for one in wrong[:10]:
    print(one)
sys.exit(1 if wrong else 0)
