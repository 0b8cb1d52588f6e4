import { describe, expect, test } from 'vitest';
import { connectionAttempts } from '../support/connection-attempts.ts';

/** Lines as strace 6.1 writes them. */
const LINES = {
  dns: '118 connect(19, {sa_family=AF_INET, sin_port=htons(53), sin_addr=inet_addr("10.255.255.53")}, 16 <unfinished ...>',
  six: '118 connect(16, {sa_family=AF_INET6, sin6_port=htons(443), sin6_flowinfo=htonl(0), inet_pton(AF_INET6, "2001:db8::88", &sin6_addr), sin6_scope_id=0}, 28) = 0',
  sent: '7 sendto(21, ""..., 40, MSG_NOSIGNAL, {sa_family=AF_INET, sin_port=htons(3478), sin_addr=inet_addr("192.0.2.1")}, 16) = 40',
  message:
    '7 sendmsg(4, {msg_name={sa_family=AF_INET, sin_port=htons(9), sin_addr=inet_addr("203.0.113.5")}, msg_namelen=16, msg_iov=[{iov_base=""..., iov_len=3}], msg_iovlen=1, msg_controllen=0, msg_flags=0}, 0) = 3',
  many: '7 sendmmsg(4, [{msg_hdr={msg_name={sa_family=AF_INET, sin_port=htons(1), sin_addr=inet_addr("192.0.2.7")}, msg_namelen=16}}, {msg_hdr={msg_name={sa_family=AF_INET, sin_port=htons(2), sin_addr=inet_addr("192.0.2.8")}, msg_namelen=16}}], 2, 0) = 2',
  loopback: '9 connect(3, {sa_family=AF_INET, sin_port=htons(8080), sin_addr=inet_addr("127.0.0.1")}, 16) = 0',
  loopbackSix:
    '9 connect(3, {sa_family=AF_INET6, sin6_port=htons(80), sin6_flowinfo=htonl(0), inet_pton(AF_INET6, "::1", &sin6_addr), sin6_scope_id=0}, 28) = 0',
  localResolver: '9 connect(3, {sa_family=AF_INET, sin_port=htons(53), sin_addr=inet_addr("127.0.0.53")}, 16) = 0',
  screen: '9 connect(3, {sa_family=AF_UNIX, sun_path=@"/tmp/.X11-unix/X3"}, 20) = 0',
  lookUp: '9 connect(3, {sa_family=AF_UNIX, sun_path="/run/systemd/resolve/io.systemd.Resolve"}, 42) = 0',
  inside: '9 sendmsg(23, {msg_name=NULL, msg_namelen=0, msg_iov=[{iov_base=""..., iov_len=96}], msg_iovlen=1}, 0) = 96',
  kernel: '9 sendto(41, [{nlmsg_len=20}], 20, 0, {sa_family=AF_NETLINK, nl_pid=0, nl_groups=00000000}, 12) = 20',
  strange: '9 connect(3, {sa_family=AF_VSOCK, svm_cid=VMADDR_CID_HOST, svm_port=0x400}, 16) = -1 ENODEV',
  unseen: '9 io_uring_setup(64, {flags=0}) = 12',
  resumed: '118 <... connect resumed>)          = 0',
};

describe('an attempt to reach somebody', () => {
  test('is every address beyond this machine, by any call, also several in one', () => {
    const { dns, six, sent, message, many } = LINES;
    expect(connectionAttempts([dns, six, sent, message, many].join('\n'))).toEqual([
      'connect 10.255.255.53 port 53',
      'connect 2001:db8::88 port 443',
      'sendto 192.0.2.1 port 3478',
      'sendmsg 203.0.113.5 port 9',
      'sendmmsg 192.0.2.7 port 1',
      'sendmmsg 192.0.2.8 port 2',
    ]);
  });

  test('is a question for a name, also where a service of this machine would carry it on', () => {
    expect(connectionAttempts([LINES.localResolver, LINES.lookUp].join('\n'))).toEqual([
      'connect 127.0.0.53 port 53',
      'connect sun_path="/run/systemd/resolve/io.systemd.Resolve"',
    ]);
  });

  test('is whatever is not known to stay here', () => {
    expect(connectionAttempts([LINES.strange, LINES.unseen].join('\n'))).toEqual([
      'connect AF_VSOCK, svm_cid=VMADDR_CID_HOST, svm_port=0x400',
      'io_uring_setup',
    ]);
  });

  test('is not what stays on this machine', () => {
    const { loopback, loopbackSix, screen, inside, kernel, resumed } = LINES;
    expect(connectionAttempts([loopback, loopbackSix, screen, inside, kernel, resumed, ''].join('\n'))).toEqual([]);
  });
});
