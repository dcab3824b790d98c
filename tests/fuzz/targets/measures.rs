#![no_main]

libfuzzer_sys::fuzz_target!(|input: &[u8]| tamis_tests::laws::measures(input));
