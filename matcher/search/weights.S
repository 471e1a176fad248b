// The weights of the matching model and of the pair network, inside the library: nothing is read from disk at run time.
    .section .rodata
    .global evet_matching_weights
    .global evet_matching_weights_end
evet_matching_weights:
    .incbin "models/weights/matching.json"
evet_matching_weights_end:
    .byte 0
    .global evet_strip_errors
    .global evet_strip_errors_end
evet_strip_errors:
    .incbin "models/weights/strip_errors.json"
evet_strip_errors_end:
    .byte 0
    .global evet_pairs_begin, evet_pairs_end
    .balign 16
evet_pairs_begin:
    .incbin "models/weights/pairs.onnx"
evet_pairs_end:
    .byte 0
    .section .note.GNU-stack,"",@progbits
