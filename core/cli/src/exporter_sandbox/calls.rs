//! The calls of the system that fail for a library, by seccomp.
//!
//! Calls that create, change or remove a file, open a socket, start a process, reach another process, or leave what the
//! kernel ends with this process. Threads are allowed. The filter holds for every thread that is started later.
// Source: seccomp(2), syscalls(2) and the page of each call, Linux man-pages.

use std::collections::BTreeMap;
use std::process;

use libc::c_long;
use seccompiler::{
    BpfProgram, Error, SeccompAction, SeccompCmpArgLen as Width, SeccompCmpOp as Is,
    SeccompCondition, SeccompFilter, SeccompRule, apply_filter,
};

type Rules = BTreeMap<i64, Vec<SeccompRule>>;

/// A condition: which argument, its width, and what it is compared with.
type Condition = (u8, Width, Is, u64);

/// The C library does without these two if the kernel does not know them. Their arguments lie where no filter can see
/// them.
const UNKNOWN: [c_long; 2] = [libc::SYS_clone3, libc::SYS_openat2];

/// Calls that always fail.
const FORBIDDEN: [c_long; 73] = [
    // Files.
    libc::SYS_unlinkat,
    libc::SYS_renameat,
    libc::SYS_renameat2,
    libc::SYS_mkdirat,
    libc::SYS_linkat,
    libc::SYS_symlinkat,
    libc::SYS_mknodat,
    libc::SYS_truncate,
    libc::SYS_fchmodat,
    libc::SYS_fchownat,
    libc::SYS_utimensat,
    libc::SYS_setxattr,
    libc::SYS_lsetxattr,
    libc::SYS_removexattr,
    libc::SYS_lremovexattr,
    libc::SYS_open_by_handle_at,
    libc::SYS_mount,
    libc::SYS_umount2,
    libc::SYS_pivot_root,
    libc::SYS_chroot,
    libc::SYS_open_tree,
    libc::SYS_move_mount,
    libc::SYS_fsopen,
    libc::SYS_swapon,
    libc::SYS_swapoff,
    // The network, and rings that pass calls by the filter.
    libc::SYS_socket,
    libc::SYS_socketpair,
    libc::SYS_connect,
    libc::SYS_bind,
    libc::SYS_listen,
    libc::SYS_accept,
    libc::SYS_accept4,
    libc::SYS_io_uring_setup,
    libc::SYS_io_uring_enter,
    libc::SYS_io_uring_register,
    // Processes.
    libc::SYS_execve,
    libc::SYS_execveat,
    libc::SYS_unshare,
    libc::SYS_setns,
    libc::SYS_setsid,
    libc::SYS_setpgid,
    libc::SYS_ptrace,
    libc::SYS_process_vm_readv,
    libc::SYS_process_vm_writev,
    libc::SYS_process_madvise,
    libc::SYS_move_pages,
    libc::SYS_migrate_pages,
    libc::SYS_kcmp,
    libc::SYS_tkill,
    libc::SYS_pidfd_open,
    libc::SYS_pidfd_getfd,
    libc::SYS_pidfd_send_signal,
    libc::SYS_setrlimit,
    libc::SYS_setpriority,
    libc::SYS_ioprio_set,
    libc::SYS_sched_setparam,
    libc::SYS_sched_setattr,
    libc::SYS_sched_setscheduler,
    // What stays in the kernel after the process.
    libc::SYS_shmget,
    libc::SYS_semget,
    libc::SYS_msgget,
    libc::SYS_mq_open,
    libc::SYS_add_key,
    libc::SYS_request_key,
    libc::SYS_keyctl,
    // The kernel itself.
    libc::SYS_bpf,
    libc::SYS_perf_event_open,
    libc::SYS_userfaultfd,
    libc::SYS_init_module,
    libc::SYS_finit_module,
    libc::SYS_delete_module,
    libc::SYS_kexec_load,
    libc::SYS_reboot,
];

/// Older calls for the same, which newer machines do not have.
#[cfg(target_arch = "x86_64")]
const FORBIDDEN_OLD: [c_long; 15] = [
    libc::SYS_fork,
    libc::SYS_vfork,
    libc::SYS_creat,
    libc::SYS_unlink,
    libc::SYS_rename,
    libc::SYS_mkdir,
    libc::SYS_rmdir,
    libc::SYS_link,
    libc::SYS_symlink,
    libc::SYS_mknod,
    libc::SYS_chmod,
    libc::SYS_chown,
    libc::SYS_lchown,
    libc::SYS_utime,
    libc::SYS_utimes,
];
#[cfg(not(target_arch = "x86_64"))]
const FORBIDDEN_OLD: [c_long; 0] = [];

/// Makes the calls fail from now on.
///
/// # Errors
/// If the kernel has no seccomp, or the machine is of a kind that the filter does not know.
pub(super) fn restrict() -> Result<(), Error> {
    let unknown = UNKNOWN.map(|call| (call, Vec::new()));
    apply(unknown.into(), libc::ENOSYS)?;
    let always = FORBIDDEN.into_iter().chain(FORBIDDEN_OLD);
    let mut rules: Rules = always.map(|call| (call, Vec::new())).collect();
    rules.extend(by_arguments()?);
    apply(rules, libc::EPERM)
}

fn apply(mut rules: Rules, error: i32) -> Result<(), Error> {
    if cfg!(target_arch = "x86_64") {
        // Source: asm/unistd.h, `__X32_SYSCALL_BIT`: the same calls of programs with short addresses.
        let short: Rules = rules
            .iter()
            .map(|(call, rule)| (call | 0x4000_0000, rule.clone()))
            .collect();
        rules.extend(short);
    }
    let machine = std::env::consts::ARCH.try_into()?;
    let failure = SeccompAction::Errno(error.unsigned_abs());
    let filter = SeccompFilter::new(rules, SeccompAction::Allow, failure, machine)?;
    let program: BpfProgram = filter.try_into()?;
    apply_filter(&program)
}

/// Calls that fail with some arguments only.
fn by_arguments() -> Result<Rules, Error> {
    let mut rules = Rules::new();
    let calls = of_processes().into_iter().chain(of_files());
    for (call, conditions) in
        calls.flat_map(|(call, any)| any.into_iter().map(move |all| (call, all)))
    {
        let conditions = conditions
            .into_iter()
            .map(|(argument, width, is, value)| SeccompCondition::new(argument, width, is, value));
        let rule = SeccompRule::new(conditions.collect::<Result<_, _>>()?)?;
        rules.entry(call).or_default().push(rule);
    }
    Ok(rules)
}

/// A call, and the lists of conditions of which one must hold as a whole.
type Conditional = (c_long, Vec<Vec<Condition>>);

fn of_processes() -> Vec<Conditional> {
    let own = u64::from(process::id());
    let other = || vec![vec![(0, Width::Dword, Is::Ne, own)]];
    let thread = Is::MaskedEq(number(libc::CLONE_THREAD));
    let neither = [own, 0].map(|process| (0, Width::Dword, Is::Ne, process));
    let ties = [libc::PR_SET_PDEATHSIG, libc::PR_SET_PTRACER].map(number);
    vec![
        (libc::SYS_clone, vec![vec![(0, Width::Dword, thread, 0)]]),
        (libc::SYS_kill, other()),
        (libc::SYS_tgkill, other()),
        (libc::SYS_rt_sigqueueinfo, other()),
        (libc::SYS_rt_tgsigqueueinfo, other()),
        (libc::SYS_sched_setaffinity, vec![neither.into()]),
        (
            libc::SYS_prlimit64,
            vec![vec![(2, Width::Qword, Is::Ne, 0)]],
        ),
        (libc::SYS_prctl, one_of(0, &ties)),
    ]
}

fn of_files() -> Vec<Conditional> {
    let owners = [number(libc::F_SETOWN), F_SETSIG, F_SETOWN_EX];
    vec![
        (libc::SYS_openat, opens_to_write(2)),
        #[cfg(target_arch = "x86_64")]
        (libc::SYS_open, opens_to_write(1)),
        // Who gets signals about a file, and words for a terminal.
        (libc::SYS_fcntl, one_of(1, &owners)),
        (libc::SYS_ioctl, one_of(1, &[TIOCSTI, FIOSETOWN, SIOCSPGRP])),
    ]
}

fn number(value: i32) -> u64 {
    u64::from(value.unsigned_abs())
}

fn one_of(argument: u8, values: &[u64]) -> Vec<Vec<Condition>> {
    let is = |value: &u64| vec![(argument, Width::Dword, Is::Eq, *value)];
    values.iter().map(is).collect()
}

// Source: asm-generic/fcntl.h, asm-generic/ioctls.h and asm-generic/sockios.h of Linux.
const F_SETSIG: u64 = 10;
const F_SETOWN_EX: u64 = 15;
const TIOCSTI: u64 = 0x5412;
const FIOSETOWN: u64 = 0x8901;
const SIOCSPGRP: u64 = 0x8902;

/// The flags of an open call that creates or changes a file.
fn opens_to_write(argument: u8) -> Vec<Vec<Condition>> {
    let flag = |mask: i32, value: i32| {
        let masked = Is::MaskedEq(number(mask));
        vec![(argument, Width::Dword, masked, number(value))]
    };
    vec![
        flag(libc::O_ACCMODE, libc::O_WRONLY),
        flag(libc::O_ACCMODE, libc::O_RDWR),
        flag(libc::O_ACCMODE, libc::O_ACCMODE),
        flag(libc::O_CREAT, libc::O_CREAT),
        flag(libc::O_TRUNC, libc::O_TRUNC),
    ]
}
