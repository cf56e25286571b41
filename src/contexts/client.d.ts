/// <reference types="@crxjs/vite-plugin/client" />
