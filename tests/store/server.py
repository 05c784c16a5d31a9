"""A PostgreSQL server of the tests' own: in a temporary folder, on a free port of the loopback."""

from __future__ import annotations

import os
import pwd
import shutil
import socket
import subprocess
import tempfile
from pathlib import Path
from typing import Any

import psycopg


def programs() -> Path | None:
    """Return the folder of the newest installed PostgreSQL's programs; None where there is none."""
    found = sorted(Path("/usr/lib/postgresql").glob("*/bin/initdb"), key=lambda path: float(path.parts[-3]))
    if found:
        return found[-1].parent
    on_path = shutil.which("initdb")
    return Path(on_path).resolve().parent if on_path else None


class Server:
    """A server that can be stopped hard and started again."""

    def __init__(self, bin: Path) -> None:
        self._bin = bin
        self._as: dict[str, Any] = {}
        if os.geteuid() == 0:
            user = pwd.getpwnam("postgres")
            self._as = {"user": user.pw_uid, "group": user.pw_gid, "extra_groups": []}
        self.folder = Path(tempfile.mkdtemp(prefix="halfdrop-pg-"))
        if self._as:
            os.chown(self.folder, self._as["user"], self._as["group"])
        with socket.socket() as free:
            free.bind(("127.0.0.1", 0))
            self.port = int(free.getsockname()[1])
        self._databases = 0
        self._free: list[str] = []
        self._lent: list[str] = []
        self._run("initdb", "-D", "data", "-U", "tester", "-A", "trust", "-E", "UTF8", "--locale=C", "-N")

    def _run(self, program: str, *args: str) -> None:
        subprocess.run(
            [self._bin / program, *args],
            cwd=self.folder,
            check=True,
            stdin=subprocess.DEVNULL,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            env={"PATH": os.environ["PATH"], "HOME": str(self.folder), "LC_ALL": "C"},
            **self._as,
        )

    def start(self) -> None:
        """Start, and return once it answers."""
        options = f"-p {self.port} -c listen_addresses=127.0.0.1 -k {self.folder} -c shared_buffers=32MB"
        self._run("pg_ctl", "-D", "data", "-w", "-t", "60", "-l", "log", "-o", options, "start")

    def stop(self) -> None:
        """Stop at once, as a power cut would: no checkpoint, no farewell to clients."""
        self._run("pg_ctl", "-D", "data", "-w", "-m", "immediate", "stop")

    def remove(self) -> None:
        """Stop, and remove its folder."""
        self.stop()
        shutil.rmtree(self.folder)

    def url(self, database: str) -> str:
        """Return the URL of one of its databases."""
        return f"postgresql://tester@127.0.0.1:{self.port}/{database}"

    def new(self) -> str:
        """Lend an empty database, one of an earlier test where there is one, and return its URL."""
        if self._free:
            name = self._free.pop()
            with psycopg.connect(self.url(name), autocommit=True) as connection:
                others = "pid != pg_backend_pid() AND datname = current_database()"
                connection.execute(
                    f"SELECT pg_terminate_backend(pid, 5000) FROM pg_stat_activity WHERE {others}"
                )
                connection.execute("DROP SCHEMA public CASCADE")
                connection.execute("CREATE SCHEMA public")
        else:
            self._databases += 1
            name = f"store{self._databases}"
            with psycopg.connect(self.url("postgres"), autocommit=True) as connection:
                connection.execute(f"CREATE DATABASE {name}")
        self._lent.append(name)
        return self.url(name)

    def take_back(self) -> None:
        """Take back all databases lent."""
        self._free += self._lent
        self._lent = []
