// The weights of the two networks of a pattern as a part of the library, so that no file has to be found at run time.
    .section .rodata
    .global evet_spots_begin, evet_spots_end, evet_embedding_begin, evet_embedding_end
    .balign 16
evet_spots_begin:
    .incbin "models/weights/spots.onnx"
evet_spots_end:
    .byte 0
    .balign 16
evet_embedding_begin:
    .incbin "models/weights/embedding.onnx"
evet_embedding_end:
    .byte 0
    .section .note.GNU-stack,"",%progbits
