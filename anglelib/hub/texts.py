"""What ``python -m anglelib hub`` writes: JupyterHub's configuration, and the instructor's instructions.

Both are templates; ``@WORD@`` stands for what is known only on the machine. The configuration has no
password, and no name of a learner: who may come in is a group of the system.
"""

CONFIG = r'''"""JupyterHub for a class: each learner in an account of the system, the lessons shared and read-only.

Written by: python -m anglelib hub. The instructions are beside it, in @INSTRUCTIONS@.
JupyterHub runs what stands here with root's rights: keep this folder writable for root alone.
"""

import ipaddress
import sys
from pathlib import Path

HERE = Path(__file__).resolve().parent
PYTHON = @PYTHON@  # the Python that the course is installed for

# ---- what you may want to change -----------------------------------------------------------------
GROUP = @GROUP@  # the accounts in this group of the system may come in, with their own passwords
ADDRESS, PORT = "127.0.0.1", 8000  # 127.0.0.1: this machine only. Any other address needs TLS
TLS_KEY, TLS_CERTIFICATE = "", ""  # the files of the key and the certificate
IDLE_PAGE = 3600  # after so long without a sign from it, a kernel without an open page is ended [s]
IDLE_LEARNER = 2 * 3600  # and so long after the last kernel, the learner's server [s]. No answer is lost by either

# ---- who may come in -----------------------------------------------------------------------------
c = get_config()  # noqa: F821
c.JupyterHub.authenticator_class = "pam"  # the system's accounts and their passwords
c.PAMAuthenticator.allowed_groups = {GROUP}
c.PAMAuthenticator.open_sessions = False
c.Authenticator.allow_all = False
c.Authenticator.admin_users = set()  # nobody sees another's server through the hub; root reads the answers

# ---- where -----------------------------------------------------------------------------------------
try:
    here_only = ipaddress.ip_address(ADDRESS).is_loopback
except ValueError:
    sys.exit(f"ADDRESS is {ADDRESS!r}: write an address of this machine in numbers, such as 127.0.0.1.")
if not here_only and not (TLS_KEY and TLS_CERTIFICATE):
    sys.exit(f"ADDRESS is {ADDRESS}, which others can reach: set TLS_KEY and TLS_CERTIFICATE, or passwords could be read on the way.")
for file in filter(None, (TLS_KEY, TLS_CERTIFICATE)):
    if not Path(file).is_file():
        sys.exit(f"{file} is not there: TLS_KEY and TLS_CERTIFICATE name two files.")
c.JupyterHub.bind_url = f"{'https' if TLS_KEY else 'http'}://{f'[{ADDRESS}]' if ':' in ADDRESS else ADDRESS}:{PORT}"
c.JupyterHub.ssl_key, c.JupyterHub.ssl_cert = TLS_KEY, TLS_CERTIFICATE
c.JupyterHub.hub_ip = "127.0.0.1"
c.JupyterHub.db_url = f"sqlite:///{HERE / 'jupyterhub.sqlite'}"
c.JupyterHub.cookie_secret_file = str(HERE / "jupyterhub_cookie_secret")
c.ConfigurableHTTPProxy.pid_file = str(HERE / "jupyterhub-proxy.pid")
proxy = HERE / "node_modules" / ".bin" / "configurable-http-proxy"
if proxy.exists():  # otherwise the one that is installed for the whole machine
    c.ConfigurableHTTPProxy.command = [str(proxy)]

# ---- a learner's server ------------------------------------------------------------------------------
c.JupyterHub.spawner_class = "jupyterhub.spawner.LocalProcessSpawner"  # with the learner's rights, in the learner's home
c.Spawner.cmd = [PYTHON, "-sP", "-m", "anglelib.hub.learner_server"]
c.Spawner.args = [
    f"--MappingKernelManager.cull_idle_timeout={IDLE_PAGE}",
    "--MappingKernelManager.cull_interval=300",
    f"--ServerApp.shutdown_no_activity_timeout={IDLE_LEARNER}",
]
c.Spawner.default_url = "/lab/tree/notebooks/@FIRST@"
c.Spawner.environment = {"PYTHONNOUSERSITE": "1"}  # only what is installed for the class
c.Spawner.disable_user_config = True  # and only its settings
c.Spawner.start_timeout = c.Spawner.http_timeout = 300  # a whole class that starts at once takes its time [s]
'''

INSTRUCTIONS = r"""# The course for a class, on one machine

Each learner works in a browser, in an account of the system with a password of its own. The lessons are shared and nobody in the class can
change them; what a learner answers or makes lies in the learner's own folder, which only that learner and root can open. The server is
JupyterHub. You need a machine with Linux on which you may use `sudo`, and one hour on the day before.

## Set up, once

1. **The project where every account can read it**, and owned by root: unpack it into `/srv/anglelib`, not into anybody's home.

   ```sh
   cd /srv/anglelib
   sudo python3 -m venv .venv
   sudo .venv/bin/python -m pip install -r requirements.txt
   sudo .venv/bin/python -m pip install -e ".[hub]"
   sudo .venv/bin/python -m compileall -q anglelib
   sudo chmod -R go=rX .
   ```

2. **This folder**, for root alone: `sudo .venv/bin/python -m anglelib hub --out /srv/anglelib-hub` wrote it, or will.

3. **The proxy**, which hands each browser to its learner's server. It comes from npm and needs Node.js (Debian, Ubuntu:
   `sudo apt install nodejs npm`):

   ```sh
   sudo npm install --prefix @FOLDER@ configurable-http-proxy
   ```

4. **The group, and an account for each learner.** `adduser` asks for a password; let the learner type it, or give each another one.

   ```sh
   sudo groupadd @GROUP@
   sudo adduser --gecos "" --ingroup @GROUP@ learner1
   ```

   For many at once, this makes passwords by chance and keeps them in a list that only root can read. Print it, cut it into slips, delete it.

   ```sh
   sudo bash -c 'umask 077; for n in $(seq 1 12); do p=$(openssl rand -base64 9) &&
     useradd -m -K HOME_MODE=0700 -g @GROUP@ -s /bin/bash "learner$n" && echo "learner$n:$p" | tee -a @FOLDER@/slips.txt | chpasswd; done'
   ```

## Start and stop

```sh
sudo @HUB@ --config @FOLDER@/jupyterhub_config.py
```

Open http://127.0.0.1:8000 on this machine and log in as a learner: lesson 00 opens. Ctrl-C stops the hub and every learner's server.

**So that other machines can reach it**, change three lines at the top of `jupyterhub_config.py`: the address, and the two files of a TLS key
and certificate. Without these two it refuses any address but this machine's own, because passwords would go over the network in the clear.
Ask whoever keeps your network for a certificate with the machine's name. For a room of your own, one that you make yourself will do; each
browser then warns once, and the learners must be told what to expect:

```sh
sudo openssl req -x509 -newkey rsa:2048 -nodes -days 30 -keyout @FOLDER@/tls.key -out @FOLDER@/tls.crt \
  -subj "/CN=classroom.lan" -addext "subjectAltName=DNS:classroom.lan"
```

Where a web server already holds the machine's certificate, leave the hub at 127.0.0.1 and let that server pass everything on to it,
websockets included. Open the hub to your own room, not to the internet.

## How big a machine

@SIZING@

The hub sets no limit to a learner's memory; the system starts to kill when it runs out, and may kill the wrong one. Have the memory that the
rule says, and some swap. A limit that is kept needs systemd's own spawner (`pip install jupyterhub-systemdspawner`, then
`spawner_class = "systemd"` and `c.SystemdSpawner.mem_limit = "1G"`; not run by us). A page that is closed ends its kernel; a kernel whose page
was left an hour ago is ended, and two hours later the learner's server; the next click starts them again, with every answer.

## In class

- **Lessons are read-only.** Everything on a page works and can be run; saving the page is refused, and when it is closed JupyterLab asks:
  *Discard* is right. Answers keep themselves. To keep a page as it stands: *File, Save Notebook As*, with a name without a folder, such as
  `my_page.ipynb`.
- **Who is stuck:** only root can open the learners' answers, which are `anglelib-course/answers` in each home. `python -m anglelib stuck`
  counts mistakes and names nobody:

  ```sh
  @STUCK@
  ```

- **A page hangs:** *Kernel, Restart Kernel and Run All Cells*; if that does not help, *File, Hub Control Panel, Stop My Server*, and start it.
- **A password is forgotten:** `sudo passwd learner1`.
- **Afterwards:** let each learner take `anglelib-course` along, then `sudo deluser --remove-home learner1`, with all of its answers.

## What is kept apart, and what is not

- Each learner's server runs with that account's rights: the system itself keeps the folders apart. A notebook can run any program, so
  whatever an account may do on this machine, its learner may do. Keep nothing on it that is open to every account and should not be.
- **`SimpleLocalProcessSpawner` and every other set-up in which all servers run in one account give no isolation at all**: each learner can
  read, change and delete everybody's answers, and stop everybody's server. Use it to look at the hub on your own, never with a class.
- Learners are taken to be a class, not attackers: all share one name in the browser's address, and the machine's processors and memory.
  JupyterHub's `subdomain_host` parts them in the browser too, and needs names from your network.

## On more than one machine

Keep the hub, the group of learners and the start of a learner's server; change where that server runs. JupyterHub has spawners for it, none
of which was run by us: DockerSpawner (containers), KubeSpawner (Kubernetes), BatchSpawner (a cluster's queue). For each:

- `c.JupyterHub.spawner_class` is its name, and its own memory and processor limits are then kept.
- The image, or each machine, holds the project and its environment at one path, owned by root and readable by all; `c.Spawner.cmd` stays.
- Each learner has a home that goes along: a volume of its own (a shared disk on a queue's machines), mode 0700; the project is mounted
  read-only. `ANGLELIB_HOME` in `c.Spawner.environment` names another folder than `anglelib-course` in the home.
- The learners' servers must reach the hub: `c.JupyterHub.hub_ip` is then the address of the machine in the cluster's own network, closed to the
  outside, with `c.JupyterHub.internal_ssl = True` or the cluster's own encryption.
- Containers know no system accounts: use the authenticator of your school's or club's log-in in place of PAM, and name who may come in.
"""
